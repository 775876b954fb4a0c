"""Files for people: presented pages rendered as one pack, or as volumes with an index."""
