"""Pure answers: which pins feed a converter, what switches it on, how loud it gets, and why."""
