-- A person's PIN, for a phone that goes from hand to hand: the hash, sealed as her name is, for the few digits of a PIN are soon found
-- from a hash alone. Null: she has none.

alter table people add column pin text;
