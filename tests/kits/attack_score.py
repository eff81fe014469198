"""The score of the attack suite: `python tests/kits/attack_score.py` prints what did not come out as expected."""

from __future__ import annotations

from attacks import HARMFUL, SOUND
from attacks.attack_kit import outcome


def main() -> None:
    right = 0
    for kind, attacks in (("harmful", HARMFUL), ("sound", SOUND)):
        wrong = [(attack.name, said) for attack in attacks if (said := outcome(attack))]
        for name, said in wrong:
            print(f"{kind}: {name}\n    {said}")
        right += len(attacks) - len(wrong)
        print(f"{kind}: {len(attacks) - len(wrong)} of {len(attacks)} as expected")
    print(f"all: {right} of {len(HARMFUL) + len(SOUND)}")


if __name__ == "__main__":
    main()
