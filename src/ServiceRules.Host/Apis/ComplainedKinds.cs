using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

/// <summary>The kinds of problem that a route may answer with, for the description of the interface.</summary>
internal sealed record ComplainedKinds(IReadOnlyList<ProblemKind> Kinds);
