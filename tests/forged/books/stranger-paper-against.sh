# ... held against the book with the others.
#= 1
#> agrees      job-record.pdf
#> contradicts painted.pdf: seal 1 is by a key that this book does not know
paint painted.pdf
forge_key eve.p12 "Rosa Muestra" "certified renovator"
seal_elsewhere painted.pdf eve.p12
M book check --against job-record.pdf painted.pdf
