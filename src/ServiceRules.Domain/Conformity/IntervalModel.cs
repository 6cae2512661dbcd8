namespace ServiceRules.Domain.Conformity;

/// <summary>What a rule takes to be so inside an interval that go/no-go tests left.</summary>
public enum IntervalModel
{
    /// <summary>Nothing: any value in it may be the true one. The default.</summary>
    None,

    /// <summary>
    /// Declared by the rule: every value equally likely (JCGM 100:2008, 4.3.7). An interval with a missing end has no such model.
    /// </summary>
    Uniform,
}
