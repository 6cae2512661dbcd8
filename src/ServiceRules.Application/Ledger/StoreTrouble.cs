namespace ServiceRules.Application.Ledger;

/// <summary>What kept a store from doing what was asked. Nothing of it was done, except where a member says otherwise.</summary>
public enum StoreTrouble
{
    /// <summary>Somebody else kept it locked for too long.</summary>
    Busy,

    /// <summary>The disk is full.</summary>
    Full,

    /// <summary>It may not be written to.</summary>
    ReadOnly,

    /// <summary>Its files are damaged, or are no ledger.</summary>
    Damaged,

    /// <summary>Its folder or key is open to others, or cannot be used.</summary>
    NotPrivate,

    /// <summary>The disk or the system failed.</summary>
    Failed,

    /// <summary>The database cannot be reached. What was under way may have been done: sent again, it is told.</summary>
    Gone,

    /// <summary>It became what this process does not take it for, since the process opened it.</summary>
    Outdated,

    /// <summary>
    /// It was done and is durable, but its checkpoint could not be kept outside. The next opening keeps it.
    /// </summary>
    NotShelved,

    /// <summary>Other rules came into force, or other waivers, each time that it was judged.</summary>
    Overtaken,

    /// <summary>What lists are made of is not what was made of the log. Nothing of it was told, and nothing rests on it.</summary>
    Rows,
}
