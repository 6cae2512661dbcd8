using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Inbox;

/// <summary>What came of a dropped file, as it is written beside it.</summary>
/// <param name="File">The file, as it was named.</param>
/// <param name="Sha256">Digest of its bytes; left out where it was not read.</param>
/// <param name="At">When it was answered, by the clock of the service.</param>
/// <param name="Outcome">Whether all of it stands, or it was set aside.</param>
internal sealed record InboxAnswer(string File, string? Sha256, DateTimeOffset At, InboxOutcome Outcome)
{
    /// <summary>Of a record: that it stands, as over HTTP.</summary>
    public SubmissionAnswer? Record { get; init; }

    /// <summary>What is wrong with the file, as over HTTP.</summary>
    public ProblemDocument? Problem { get; init; }

    /// <summary>Of a table: what came of each of its records.</summary>
    public IReadOnlyList<ToldImport>? Records { get; init; }

    /// <summary>Of a table: what is wrong with it as a whole, so that nothing of it was filed.</summary>
    public IReadOnlyList<ToldRow>? Rows { get; init; }
}
