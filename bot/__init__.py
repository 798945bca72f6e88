"""How a question is asked and an answer shown: Discord, a local chat, a command line. No arithmetic."""
