namespace ServiceRules.Application.RuleCases.Mutation;

/// <summary>What became of a changed folder of rules.</summary>
public enum MutantEnd
{
    /// <summary>A case, or a fixture that no longer may go out, tells of it.</summary>
    Caught,

    /// <summary>No case tells, and the check of the folder refuses it: it can never be in force.</summary>
    Refused,

    /// <summary>No case tells, and one shows that the change makes no difference: the check is silent there anyway.</summary>
    Alike,

    /// <summary>Nothing tells.</summary>
    Survived,

    /// <summary>It was not tried any more.</summary>
    NotTried,
}
