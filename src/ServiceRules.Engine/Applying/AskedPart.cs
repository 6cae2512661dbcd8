namespace ServiceRules.Engine.Applying;

/// <summary>One part of when a rule applies, as its file names it.</summary>
public enum AskedPart
{
    /// <summary>The first day in force.</summary>
    From,

    /// <summary>The last day in force.</summary>
    Until,

    /// <summary>Where the work is done.</summary>
    Place,

    /// <summary>Whether there is something to switch off.</summary>
    Isolation,

    /// <summary>The area that the machine serves.</summary>
    Areas,

    /// <summary>The tasks of the job or unit.</summary>
    Tasks,

    /// <summary>What was read and still holds, whatever the tasks: what lets a rule in that the tasks would keep out.</summary>
    OrRead,

    /// <summary>The limit sheet of the unit.</summary>
    Sheets,

    /// <summary>How the bedknife is mounted.</summary>
    Bedknife,

    /// <summary>What is fitted.</summary>
    Attachments,

    /// <summary>The school in force.</summary>
    School,

    /// <summary>What was turned.</summary>
    AnyTurned,

    /// <summary>What was read.</summary>
    AnyRead,

    /// <summary>What was read at two places or more along the width.</summary>
    AnyReadAlong,

    /// <summary>Whether metal was removed.</summary>
    Ground,

    /// <summary>Whether the sheet states what the check needs.</summary>
    SheetStates,
}
