-- Saves the session, remembers the reply and gives the lock back, if the lock is still held by this token.
--
-- KEYS[1]  the reply remembered for this message
-- KEYS[2]  the phone's lock
-- KEYS[3]  the phone's session
-- KEYS[4]  the reply remembered for a moment for a message like this one under any id
-- ARGV[1]  the token the lock was taken with
-- ARGV[2]  the session
-- ARGV[3]  the session's time to live, milliseconds
-- ARGV[4]  the reply
-- ARGV[5]  the reply's time to live, milliseconds
-- ARGV[6]  how long that moment is, milliseconds; 0: there is none
--
-- Returns  1 written | 0 the lock was no longer ours and nothing was written
--
-- A close that is sent again after a lost connection finds its lock gone and returns 0. The caller then opens again
-- and gets the reply from memory, so nothing is done twice.

if redis.call('GET', KEYS[2]) ~= ARGV[1] then
  return 0
end

redis.call('SET', KEYS[3], ARGV[2], 'PX', ARGV[3])
redis.call('SET', KEYS[1], ARGV[4], 'PX', ARGV[5])
if tonumber(ARGV[6]) > 0 then
  redis.call('SET', KEYS[4], ARGV[4], 'PX', ARGV[6])
end
redis.call('DEL', KEYS[2])
return 1
