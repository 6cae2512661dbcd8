namespace ServiceRules.Domain.Wear;

/// <summary>From which side wear comes to a limit.</summary>
public enum LimitSide
{
    /// <summary>The value shrinks to it: a diameter, a lip.</summary>
    Lower,

    /// <summary>The value grows to it: a land, a gap.</summary>
    Upper,
}
