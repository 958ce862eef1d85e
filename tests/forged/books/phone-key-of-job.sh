# ... and says that it is of the job.
#= 3
#> a.entries, entry phone/1: it is the firm's and names a job
phone a.entries J-1926 phone rosa device_key '{"device":"phone","key":"0000000000000000000000000000000000000000000000000000000000000007"}'
M entry import a.entries
