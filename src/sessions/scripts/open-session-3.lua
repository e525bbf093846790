-- Answers a repeated message from memory, or takes the phone's lock and loads its session.
--
-- KEYS[1]  the reply remembered for this message
-- KEYS[2]  the phone's lock
-- KEYS[3]  the phone's session
-- ARGV[1]  the token to take the lock with
-- ARGV[2]  the lock's time to live, milliseconds
--
-- Returns  {'repeated', reply} | {'busy'} | {'held', session or nil}

local reply = redis.call('GET', KEYS[1])
if reply then
  return { 'repeated', reply }
end

-- Our own token already there: the client sent this command again after a lost connection.
local holder = redis.call('GET', KEYS[2])
if holder and holder ~= ARGV[1] then
  return { 'busy' }
end

redis.call('SET', KEYS[2], ARGV[1], 'PX', ARGV[2])
return { 'held', redis.call('GET', KEYS[3]) }
