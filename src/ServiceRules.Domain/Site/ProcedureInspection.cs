using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Site;

/// <summary>The certificate of a periodic inspection of a procedure. What is absent the certificate does not state.</summary>
/// <param name="On">The day of the inspection.</param>
/// <param name="Inspector">Who inspected.</param>
/// <param name="Machine">On which machine the procedure was seen in use.</param>
/// <param name="People">The people with whom their duties were gone through.</param>
/// <param name="Users">The people who use the procedure; an inspector is none of them.</param>
/// <param name="TagLimitsReviewed">The limits of tags were gone through as well.</param>
/// <param name="Findings">What was found wrong.</param>
public sealed record ProcedureInspection(
    DateOnly On,
    Id<Participant>? Inspector,
    Id<MachineVisit>? Machine,
    ImmutableArray<Id<Participant>> People,
    ImmutableArray<Id<Participant>> Users,
    bool TagLimitsReviewed,
    ImmutableArray<InspectionFinding> Findings
);
