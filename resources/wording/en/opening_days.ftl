# Days the shop is open, and days that are planned.
closed = closed
moment = moment
moment_accepted = a time with its offset is accepted
last_day = last day
day_not_before = a day not before the first one is accepted
day_from_today = a day from today on is accepted
day_within = a day within { $days } days is accepted; no date is worked out beyond that
holidays_of_shop = holidays of the shop
holidays_accepted = a country (ISO 3166, like US) and one of its states or provinces are accepted
