
-- ---- for the office: views to read, of the firm of whoever asks. Nothing is judged from them:
-- what is due, and whether a job may go on, is asked of the program. ------------------------------
CREATE VIEW mistfold_office.entry WITH (security_barrier) AS
  SELECT e.device || '/' || e.seq AS entry, e.at, e.who, e.kind, e.job, e.body::jsonb AS body,
         e.device, e.seq
    FROM mistfold.entry e WHERE e.firm = (SELECT mistfold.my_firm());
