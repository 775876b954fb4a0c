"""Setting out: the limits of practice used forwards, before the work, to say where to cut and drill.

Numbers and small frozen values in, the same out. Everything here is in whole millimetres, because that is
what a tape shows; the limits come in as :class:`~revealbook.setting_out.limits.Limits`, filled by the caller
from the rule set in force. Where no layout keeps every limit, a
:class:`~revealbook.setting_out.refusal.NotPossible` comes back instead of an answer.
"""
