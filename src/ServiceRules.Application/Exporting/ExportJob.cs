using ServiceRules.Evidence;

namespace ServiceRules.Application.Exporting;

/// <summary>A list that somebody wants as a file.</summary>
/// <param name="Id">Drawn for it.</param>
/// <param name="By">Who asked, as acts name it: nobody else gets it.</param>
/// <param name="Request">What was asked, as a document of its own format.</param>
/// <param name="AskedAt">When.</param>
/// <param name="ExpiresAt">When it is removed.</param>
public sealed record ExportJob(
    string Id,
    string By,
    string Request,
    DateTimeOffset AskedAt,
    DateTimeOffset ExpiresAt
)
{
    /// <summary>The site whose records whoever asked sees; null: of none.</summary>
    public string? Site { get; init; }

    public ExportState State { get; init; }

    /// <summary>Rows that are written.</summary>
    public long Rows { get; init; }

    /// <summary>Bytes that are written.</summary>
    public long Bytes { get; init; }

    /// <summary>Digest of the file, once it is whole.</summary>
    public ContentHash? Digest { get; init; }

    /// <summary>Why there will be no file.</summary>
    public string? Failure { get; init; }
}
