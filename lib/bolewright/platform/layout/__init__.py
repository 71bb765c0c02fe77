"""Where every part is: members, seats, boards, guards, stairs, openings; what each brings to the framing at a place."""
