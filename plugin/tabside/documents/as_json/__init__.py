"""What `--json` answers: the craft's model, the verdict, the plan and the proof as data."""
