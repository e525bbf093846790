-- The entries that were kept first.
--
-- KEYS[1]  keys of the entries in the order they came (sorted set)
-- KEYS[2]  the entries by key (hash)
-- ARGV[1]  how many at most
--
-- Returns  their texts, oldest first

local keys = redis.call('ZRANGE', KEYS[1], 0, tonumber(ARGV[1]) - 1)
if #keys == 0 then
  return {}
end
return redis.call('HMGET', KEYS[2], unpack(keys))
