namespace ServiceRules.Application.Filed;

/// <summary>The file in which a record's context lies beside it.</summary>
public static class ContextFile
{
    private const string Record = ".record.json";

    /// <summary>Where the context of the record in a file would lie.</summary>
    public static string Beside(string file)
    {
        ArgumentNullException.ThrowIfNull(file);
        var stem = file.EndsWith(Record, StringComparison.OrdinalIgnoreCase)
            ? file[..^Record.Length]
            : Path.ChangeExtension(file, null);
        return stem + FileListing.ContextEnding;
    }
}
