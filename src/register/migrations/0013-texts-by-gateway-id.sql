-- A gateway that reports a text by its own id alone: the text is found by it. Many texts of one gateway have none yet.

create index texts_out_gateway_id on texts_out (gateway_id) where gateway_id is not null;
