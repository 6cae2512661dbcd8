using System.Collections.Immutable;
using ServiceRules.Formats.Cases;

namespace ServiceRules.Application.Authoring;

/// <summary>A change of a fixture that may bring a rule to some verdict.</summary>
/// <param name="Name">What is changed, as a case says it.</param>
/// <param name="Patch">The change.</param>
internal sealed record CaseSketch(string Name, ImmutableArray<PatchStep> Patch);
