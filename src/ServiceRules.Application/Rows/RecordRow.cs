using System.Collections.Immutable;

namespace ServiceRules.Application.Rows;

/// <summary>
/// What is asked of one version of a record. Everything in it comes from the log and its contents, in the words of the
/// formats; people stand in it by pseudonym.
/// </summary>
/// <param name="Index">Place of the version in the log.</param>
/// <param name="Record">Identity of the record.</param>
/// <param name="Machine">The machine.</param>
/// <param name="Day">The day of the job in the zone of the site.</param>
/// <param name="FiledAt">When it was filed.</param>
/// <param name="RecordHash">Digest of its content.</param>
public sealed record RecordRow(
    long Index,
    string Record,
    string Machine,
    DateOnly Day,
    DateTimeOffset FiledAt,
    string RecordHash
)
{
    /// <summary>The site whose registers judged it; null when the context was gone before this was ever read.</summary>
    public string? Site { get; init; }

    /// <summary>The turf area that the machine serves.</summary>
    public string? Area { get; init; }

    public ImmutableArray<string> Tasks { get; init; } = [];

    /// <summary>Pseudonym of who answers for it.</summary>
    public string? By { get; init; }

    /// <summary>Whether it corrects an earlier version.</summary>
    public bool IsAmendment { get; init; }

    /// <summary>Whether no version of the record came after it.</summary>
    public bool IsNewest { get; init; }

    /// <summary>Whether it is open, signed off or followed up.</summary>
    public required string State { get; init; }

    /// <summary>Whether the job may go out; null when its assessment is gone.</summary>
    public string? Disposition { get; init; }

    /// <summary>Place of its newest assessment in the log; null when that is gone.</summary>
    public long? AssessmentIndex { get; init; }

    /// <summary>Digest of that assessment.</summary>
    public string? AssessmentHash { get; init; }

    public bool Equals(RecordRow? other) =>
        other is not null
        && (Index, Record, Machine, Day, FiledAt, RecordHash)
            == (other.Index, other.Record, other.Machine, other.Day, other.FiledAt, other.RecordHash)
        && (Site, Area, By, IsAmendment, IsNewest)
            == (other.Site, other.Area, other.By, other.IsAmendment, other.IsNewest)
        && (State, Disposition, AssessmentIndex, AssessmentHash)
            == (other.State, other.Disposition, other.AssessmentIndex, other.AssessmentHash)
        && Tasks.SequenceEqual(other.Tasks);

    public override int GetHashCode() => HashCode.Combine(Index, RecordHash, AssessmentHash);
}
