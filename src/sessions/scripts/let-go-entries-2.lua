-- Lets entries go that are written elsewhere by now.
--
-- KEYS[1]  keys of the entries in the order they came (sorted set)
-- KEYS[2]  the entries by key (hash)
-- ARGV     keys of the entries

for _, key in ipairs(ARGV) do
  redis.call('ZREM', KEYS[1], key)
  redis.call('HDEL', KEYS[2], key)
end
