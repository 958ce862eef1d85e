# The book is rewritten, and the heads that the entries of seals name are left as they were.
#= 1
#> entry office/417: the head @ of its paper is not that of the entries it names
reading_changed
M book check
