-- Gives the lock back without writing, if it is still held by this token.
--
-- KEYS[1]  the phone's lock
-- ARGV[1]  the token the lock was taken with
--
-- Returns  1 given back | 0 it was no longer ours

if redis.call('GET', KEYS[1]) ~= ARGV[1] then
  return 0
end
return redis.call('DEL', KEYS[1])
