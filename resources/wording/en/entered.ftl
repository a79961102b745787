# Text a person typed: what is accepted, wherever it is typed.

printable = only characters that can be printed are accepted
one_line = one line of text is accepted
most_letters = up to { $most } letters are accepted
few_words = a few words are needed
