namespace ServiceRules.Application.Filed;

/// <summary>The records behind some paths.</summary>
/// <param name="gathering">Looks through them.</param>
/// <param name="paths">Files and folders.</param>
public sealed class RecordsInFiles(RecordGathering gathering, IEnumerable<string> paths) : IRecordSource
{
    public Gathered<T> Gather<T>(Func<FiledRecord, T?> keep)
        where T : class => gathering.Gather(paths, keep);
}
