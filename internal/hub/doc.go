// Package hub is the sync: phones send what they did and fetch what others did,
// through one log with one cursor.
//
// Enter by [New] and [Hub.Sync], which sends and fetches in one exchange and can
// be repeated without harm; [Hub.Watch] and [Hub.News] tell when there is more
// to fetch. A reply acknowledges only what is on disk. What can't be taken is
// refused with its reason, never taken in part.
//
// An event's stamp is final once the server has the event: a stamp too far ahead
// of the server's clock is replaced, see dinner.Final. Files edited on two
// devices are merged by line, see package merge; where lines clash, both versions
// are kept beside each other for somebody to choose.
//
// The package may import merge, dinner and store. It reads no clock of its own:
// [New] is given one.
package hub
