using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.RuleCases;

/// <summary>Whether a fixture, as it stands, may go out: cases start from records with nothing wrong.</summary>
/// <param name="Fixture">Its name.</param>
/// <param name="File">Its record, relative to the folder of rules.</param>
/// <param name="IsReleased">Whether every unit and the job may go out.</param>
/// <param name="Told">What keeps it, or why it cannot be read; empty when it is released.</param>
public sealed record FixtureResult(string Fixture, string File, bool IsReleased, ImmutableArray<string> Told)
{
    /// <summary>The record and context as they stand; null when they cannot be read.</summary>
    internal (ServiceRecord Record, AssessmentContext Context)? Built { get; init; }

    /// <summary>Whether an assessment lets the job and every unit go out.</summary>
    internal static bool IsReleasedBy(Assessment assessment) =>
        assessment.Job.Disposition is Disposition.Release
        && assessment.Units.All(unit => unit.Outcome.Disposition is Disposition.Release);
}
