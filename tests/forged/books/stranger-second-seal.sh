# A second seal is put in the firm's place of the true record, by a key in the firm's name.
#= 1
#> seal 1       logged as office/417, renovator
#> seal 2       NOT GOOD HERE: is not logged in this book, which does not know its key
#> seal 2 is by a key that this book does not know
seal_as_firm job-record.pdf
M paper check job-record.pdf --compare
