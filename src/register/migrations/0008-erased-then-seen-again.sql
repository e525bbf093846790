-- When a baby was erased: what was said of it before is not written any more, what is said of it later is a new record.
alter table babies add column erased_at bigint;
update babies set erased_at = (
  select max(at) from audit where what = 'baby-erased' and about = encode(sha256(convert_to(babies.id, 'UTF8')), 'hex'))
  where status = 'erased';

-- What a text cost stays counted when its words are erased.
alter table texts_out add column segments smallint;

-- For the figures of a period, and for what is erased by age.
create index babies_by_first_seen on babies (first_at);
create index referrals_by_baby on referrals (baby, at);
create index due_work_missed on due_work (due_at) where state = 'missed';
create index due_work_contacts on due_work (((body ->> 'to')::bigint)) where work = 'contact';
