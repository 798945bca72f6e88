"""What is true about weights: quantities, questions, answers. No discord, no network, no clock."""
