"""Studies of a job: attachment spacing, headroom and sensitivity to the inputs."""
