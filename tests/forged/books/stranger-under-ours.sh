# A stranger's paper is brought to the renovator, who seals it as the second: logged it is, and
# the first seal is nobody's all the same.
#= 1
#> seal 1       NOT GOOD HERE
#> seal 2       logged as office/419
paint painted.pdf
seal_as_firm painted.pdf
quietly ours paper seal painted.pdf --key rosa.p12 --as renovator
M paper check painted.pdf --compare
