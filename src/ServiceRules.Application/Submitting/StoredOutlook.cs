using System.Collections.Immutable;
using ServiceRules.Application.Assessing;

namespace ServiceRules.Application.Submitting;

/// <summary>What a record comes to, knowing what is stored, and what stored records come to knowing it.</summary>
/// <param name="Outcome">What judging it came to.</param>
/// <param name="Turned">Stored records that are judged otherwise, in the order in which they were filed.</param>
/// <param name="Size">How many entries the log had then: what was filed since may bear on it.</param>
internal sealed record StoredOutlook(AssessOutcome Outcome, ImmutableArray<JudgedAgain> Turned, long Size);
