using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Planning;

/// <summary>Concludes that the applicability of this number matched.</summary>
internal sealed record Match(int Applicability) : IConsequence<SubjectProfile>
{
    public IEnumerable<Fact> Of(SubjectProfile fact) => [new Matched(Applicability)];
}
