using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Ledger;

/// <summary>One version of something that was filed, and what came of it.</summary>
/// <param name="Entry">Its entry.</param>
/// <param name="Person">Who answers for it; null when nobody is named, or the person was forgotten.</param>
/// <param name="Changes">What changed since the version before; null for the first, or when a content is gone.</param>
/// <param name="Content">Its bytes as they were filed; null when there are none any more.</param>
/// <param name="WhyNone">Why there are none; null when there are.</param>
/// <param name="Assessments">What judging it came to, the oldest first.</param>
/// <param name="Reports">Reports that were issued on it.</param>
/// <param name="Verdicts">Findings and dispositions that are others than with the version before.</param>
public sealed record SubjectVersion(
    FiledEntry Entry,
    string? Person,
    ImmutableArray<JsonChange>? Changes,
    ReadOnlyMemory<byte>? Content,
    string? WhyNone,
    ImmutableArray<SubjectVersion.Judged> Assessments,
    ImmutableArray<FiledEntry> Reports,
    ImmutableArray<VerdictChange> Verdicts
)
{
    /// <summary>Whether a content is not there, or not as it was filed, that no erasure removed.</summary>
    public bool IsDamaged { get; init; }

    /// <summary>The person whom the account or key stands for that sent it; null: nobody, or the person was forgotten.</summary>
    public string? SentFor { get; init; }

    /// <summary>Who sent it to a service, in words; null where the entry names nobody, since no sign-in was checked.</summary>
    /// <param name="namesPerson">Whether the person is named whom the account or key stands for, or is but a pseudonym.</param>
    public string? Sent(bool namesPerson)
    {
        if (Entry.Entry.Sender is not { } sender)
        {
            return null;
        }

        var how = sender.IsKey
            ? $"sent to the service with {sender.Name}"
            : $"sent to the service by {sender.Name}, which had signed in";
        return sender.Person is not { } pseudonym ? how
            : !namesPerson ? $"{how}; it stands for {pseudonym}"
            : SentFor is { } person ? $"{how}; it stands for {person} ({pseudonym})"
            : $"{how}; it stands for {pseudonym} (forgotten)";
    }

    /// <summary>One assessment of the version.</summary>
    /// <param name="Entry">Its entry.</param>
    /// <param name="Assessment">The assessment; null when it cannot be told.</param>
    /// <param name="WhyNone">Why not; null when it is there.</param>
    public sealed record Judged(FiledEntry Entry, Assessment? Assessment, string? WhyNone);
}
