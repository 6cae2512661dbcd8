namespace ServiceRules.Domain.Conformity;

/// <summary>
/// Equality at a limit: the sources leave it open (ILAC-G8:09/2019, 4.2.3), so it is a setting with a name, decided in
/// exact decimals.
/// </summary>
public enum LimitItself
{
    /// <summary>A value on the limit keeps it: "at most", "at least". The default.</summary>
    Permitted,

    /// <summary>A value on the limit breaks it: "below", "above".</summary>
    Excluded,
}
