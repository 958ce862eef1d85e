# The bytes of what was attached are changed on their way.
#= 3
#> a.entries:2: this attachment was altered: its bytes do not give its SHA-256
phone a.entries J-1926 phone rosa attachment @summary.pdf
sed -i 's/"base64":"JVBERi0/"base64":"JVBERj0/' a.entries
M entry import a.entries
