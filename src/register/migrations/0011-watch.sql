-- For the console, which lists what is open, what was closed lately and what failed, and shows one baby's course.

create index alerts_watched on alerts (state, at, key) where state <> 'closed';
create index alerts_by_baby on alerts (baby, at);
create index alert_history_closed on alert_history (at, alert) where state_to = 'closed';
create index referrals_watched on referrals (urgency desc, at, key) where state <> 'closed';
create index referrals_closed on referrals (closed_at, key) where state = 'closed';
create index due_work_by_baby on due_work (baby, due_at);
create index texts_out_failed on texts_out (at, key) where state in ('given-up', 'undelivered', 'unknown');
-- A code is looked for by its beginning, whatever the order of letters of the database.
create index babies_by_code on babies (code text_pattern_ops);
