namespace ServiceRules.Application.Rows;

/// <summary>What a record shows something of, so that it may bear on others.</summary>
public enum ShownKind
{
    /// <summary>Its machine.</summary>
    Machine,

    /// <summary>A lock or tag that an entry of its timeline names.</summary>
    Lock,

    /// <summary>Somebody who made an entry of its timeline.</summary>
    Person,

    /// <summary>A safety defect found or put right, by its machine.</summary>
    Defect,

    /// <summary>A lock or tag taken off by an exception: whoever hung it is looked for everywhere. Its key is empty.</summary>
    Exception,
}
