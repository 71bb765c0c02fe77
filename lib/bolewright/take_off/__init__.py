"""Take-off: what to cut, what to buy, what to lift, from the same layout as the checks."""
