-- Keeps entries by key, each behind those kept before it. One that is kept already stays as it is.
--
-- KEYS[1]  keys of the entries in the order they came (sorted set)
-- KEYS[2]  the entries by key (hash)
-- ARGV     key, entry, key, entry, ...
--
-- Neither key expires: what waits here is nowhere else.

local last = redis.call('ZREVRANGE', KEYS[1], 0, 0, 'WITHSCORES')
local place = tonumber(last[2] or 0)
for at = 1, #ARGV, 2 do
  if redis.call('HSETNX', KEYS[2], ARGV[at], ARGV[at + 1]) == 1 then
    place = place + 1
    redis.call('ZADD', KEYS[1], place, ARGV[at])
  end
end
