"""What ships for testing and showing: demo scripts, a player in virtual time, a playbook."""
