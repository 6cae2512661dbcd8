using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>Hands at a unit by a bench entry that says whose they were, and not when.</summary>
/// <param name="Person">Whose.</param>
/// <param name="What">What was done, after <c>the record shows</c>.</param>
/// <param name="Pointer">Where it stands in the record.</param>
internal sealed record HandsWithoutTime(Id<Participant> Person, string What, string Pointer);
