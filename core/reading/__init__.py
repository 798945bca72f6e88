"""From plain words to a question: amounts, what each is of, and what is asked."""
