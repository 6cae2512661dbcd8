using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Site;

/// <summary>A dated, reasoned loosening of one rule by another person; told in every finding it touches.</summary>
public sealed record Waiver(
    string Rule,
    string? Unit,
    Id<Participant> By,
    string Reason,
    DateOnly From,
    DateOnly Until
);
