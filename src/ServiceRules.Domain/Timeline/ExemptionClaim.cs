using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Timeline;

/// <summary>What is said for an exemption; what is not said does not count in its favour.</summary>
/// <param name="Kind">Which exemption.</param>
/// <param name="Routine">The task is routine; absent: not said.</param>
/// <param name="Repetitive">The task comes again and again; absent: not said.</param>
/// <param name="Integral">The task is part of using the machine; absent: not said.</param>
/// <param name="Facts">The eight answers that a machine without a written procedure needs.</param>
/// <param name="DecidedBy">Who decided it.</param>
/// <param name="Ground">On what ground.</param>
public sealed record ExemptionClaim(
    ExemptionKind Kind,
    bool? Routine = null,
    bool? Repetitive = null,
    bool? Integral = null,
    UndocumentedFacts? Facts = null,
    Id<Participant>? DecidedBy = null,
    string? Ground = null
);
