namespace ServiceRules.Application.Filed;

/// <summary>Where many records come from: files, or a log.</summary>
public interface IRecordSource
{
    /// <summary>Goes through them one at a time, and keeps of each only what is asked for.</summary>
    /// <param name="keep">What to keep of a record; null: nothing.</param>
    Gathered<T> Gather<T>(Func<FiledRecord, T?> keep)
        where T : class;
}
