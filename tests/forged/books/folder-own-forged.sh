# Who can write to the folder goes on with the chain of the office, without its key, and the
# office takes it for what a book that was put back lacks.
#= 3
#> refused @office/421 to 421@the chain of office, as it comes in, does not end as this device signed it
#> taken over   entries: 0, attachments: 0
unsigned_own
meet demo --adopt "the disk was lost, the book is that of the backup"
