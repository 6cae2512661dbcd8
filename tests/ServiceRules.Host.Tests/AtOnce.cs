// Many of these wait for work in the background: more of them at once than there are processors.
[assembly: CollectionBehavior(MaxParallelThreads = 3)]
