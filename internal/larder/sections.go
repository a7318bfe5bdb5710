package larder

// Sections are the sections of a shop in the order in which they are bought: what keeps
// first, what must stay cold last. Common practice, no source.
var Sections = []string{"dry goods", "oils and vinegars", "tins and jars", "drinks", "vegetables", "fruit", "herbs", "bread", "other", "dairy and eggs", "meat", "fish", "frozen"}
