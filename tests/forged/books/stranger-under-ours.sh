# A stranger's paper is brought to the renovator, who seals it as the second: logged it is, and
# the first seal is nobody's all the same.
#= 1
#> seal 1       NOT GOOD HERE
#> seal 2       logged as office/416
paint painted.pdf
forge_key eve.p12 "Muster Sash & Door (invented)" ""
seal_elsewhere painted.pdf eve.p12 --as firm
cp "$SAMPLE/passphrase.txt" pass
quietly M paper seal painted.pdf --key rosa.p12 --as renovator --passphrase-fd 3 3<pass
M paper check painted.pdf --compare
