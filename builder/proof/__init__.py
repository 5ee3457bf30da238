"""What readings prove: signatures, judging, grading, poses, scopes and unknown cavities."""
