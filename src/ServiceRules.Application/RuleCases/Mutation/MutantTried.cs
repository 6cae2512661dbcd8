namespace ServiceRules.Application.RuleCases.Mutation;

/// <summary>A changed folder of rules and what became of it.</summary>
/// <param name="Mutant">The change.</param>
/// <param name="End">What became of it.</param>
/// <param name="By">The case, fixture or diagnostic that tells; empty when nothing does.</param>
public sealed record MutantTried(Mutant Mutant, MutantEnd End, string By);
