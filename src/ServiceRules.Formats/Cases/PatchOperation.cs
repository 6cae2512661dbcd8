namespace ServiceRules.Formats.Cases;

/// <summary>What one step of a JSON Patch does (RFC 6902).</summary>
public enum PatchOperation
{
    /// <summary>Puts a value in: a new member, or into a list before the place named (`-`: at its end).</summary>
    Add,

    /// <summary>Takes a value out.</summary>
    Remove,

    /// <summary>Puts a value in the place of the one that is there.</summary>
    Replace,

    /// <summary>Takes a value from one place and puts it in another.</summary>
    Move,

    /// <summary>Puts a copy of a value in another place.</summary>
    Copy,

    /// <summary>Goes on only where the value is this one.</summary>
    Test,
}
