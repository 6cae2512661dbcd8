using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Site;

namespace ServiceRules.Rules.Model;

/// <summary>How one school sets and proves the clearance.</summary>
/// <param name="School">The school.</param>
/// <param name="Passes">Feeler that must just pass at every station; air gap only.</param>
/// <param name="Stops">Next feeler, that must not pass; air gap only.</param>
public sealed record SchoolProcedure(ContactSchool School, DualPrint? Passes, DualPrint? Stops);
