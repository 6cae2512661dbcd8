using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Site;

/// <summary>Something that a periodic inspection of a procedure found wrong.</summary>
/// <param name="Id">Its name in the certificate.</param>
/// <param name="About">The person whose work it is about; absent: about the procedure.</param>
/// <param name="Raised">When it was found.</param>
/// <param name="Due">Until when it is to be put right; absent: not stated.</param>
/// <param name="Closed">When it was put right; absent: it is open.</param>
public sealed record InspectionFinding(
    string Id,
    Id<Participant>? About,
    DateOnly Raised,
    DateOnly? Due,
    DateOnly? Closed
);
