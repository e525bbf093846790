-- When somebody was told of an urgent text that was lost. Those lost before this was noted are history.
alter table texts_out add column lost_told_at bigint;
update texts_out set lost_told_at = coalesce(settled_at, at) where urgent and state in ('given-up', 'undelivered');
create index texts_out_lost on texts_out (at, key) where urgent and state in ('given-up', 'undelivered') and lost_told_at is null;
