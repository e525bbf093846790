-- Answers a repeated message from memory, or takes the phone's lock and loads its session.
--
-- KEYS[1]  the reply remembered for this message
-- KEYS[2]  the phone's lock
-- KEYS[3]  the phone's session
-- KEYS[4]  the reply remembered for a moment for a message like this one under any id; KEYS[1] again where there is none
-- ARGV[1]  the token to take the lock with
-- ARGV[2]  the lock's time to live, milliseconds
-- ARGV[3]  a reply's time to live, milliseconds
--
-- Returns  {'repeated', reply} | {'busy'} | {'held', session or nil}

local reply = redis.call('GET', KEYS[1])
if reply then
  return { 'repeated', reply }
end

-- The same message under another id, seconds after the first: from now on its own id is known too.
local alike = redis.call('GET', KEYS[4])
if alike then
  redis.call('SET', KEYS[1], alike, 'PX', ARGV[3])
  return { 'repeated', alike }
end

-- Our own token already there: the client sent this command again after a lost connection.
local holder = redis.call('GET', KEYS[2])
if holder and holder ~= ARGV[1] then
  return { 'busy' }
end

redis.call('SET', KEYS[2], ARGV[1], 'PX', ARGV[2])
return { 'held', redis.call('GET', KEYS[3]) }
