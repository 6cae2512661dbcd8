using System.Collections.Immutable;

namespace ServiceRules.Application.RuleCases;

/// <summary>Whether a fixture, as it stands, may go out: cases start from records with nothing wrong.</summary>
/// <param name="Fixture">Its name.</param>
/// <param name="File">Its record, relative to the folder of rules.</param>
/// <param name="IsReleased">Whether every unit and the job may go out.</param>
/// <param name="Told">What keeps it, or why it cannot be read; empty when it is released.</param>
public sealed record FixtureResult(string Fixture, string File, bool IsReleased, ImmutableArray<string> Told);
