"""What the formula language cannot say: two places of each point of a table, fitted over each other as rigid bodies.

`answers` is the way in for what asks a calculator, `compiling` for what compiles one; the two do not know each other.
"""
