-- The baby that a text speaks of. Of texts from before only the key tells, and it holds the baby's id where it does.
alter table texts_out add column baby text;
create index texts_out_by_baby on texts_out (baby) where baby is not null;
