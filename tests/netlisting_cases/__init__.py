"""Small drawings, each with the verdict that KiCad gives on it: which pins share a net, and what the net is called.

The verdicts are typed, not produced: they were seen in KiCad 9.0.8, and are judged by the KiCad of the machine again
wherever there is one.
"""
