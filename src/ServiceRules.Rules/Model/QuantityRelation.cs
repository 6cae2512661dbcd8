namespace ServiceRules.Rules.Model;

/// <summary>How one quantity must stand to another.</summary>
public enum QuantityRelation
{
    /// <summary>Equal, within the allowance.</summary>
    EqualTo,

    /// <summary>Not above the other by more than the allowance.</summary>
    NotAbove,
}
