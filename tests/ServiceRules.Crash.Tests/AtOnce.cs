// Most of these wait for a program to start, or for one that died to be missed: more of them at once than there are processors.
[assembly: CollectionBehavior(MaxParallelThreads = 3)]
