# A login that may bring others' chains makes up a device.
firm; quietly M office book copy eve.book --device eve; opening eve W66; mkdir o
python3 $FORGED/segment.py eve.book eve 1 o office; python3 $PUT office 1 o/office/*
answer 1 'this book knows no device eve' meet truck
not lists truck W66
