namespace ServiceRules.Application.Comparing;

/// <summary>What kind of thing two folders of rules say differently.</summary>
public enum ChangeKind
{
    /// <summary>A rule is new.</summary>
    RuleAdded,

    /// <summary>A rule is gone.</summary>
    RuleRemoved,

    /// <summary>When a rule applies.</summary>
    Condition,

    /// <summary>What a rule checks, or on what it is judged.</summary>
    Check,

    /// <summary>How measured values are decided.</summary>
    Decision,

    /// <summary>How much a breach weighs, or what happens to what cannot be proven.</summary>
    Severity,

    /// <summary>What a limit sheet asks of a quantity.</summary>
    Limit,

    /// <summary>What else a limit sheet says of its kind of unit: adjusters, sizes, wear.</summary>
    UnitKind,

    /// <summary>A limit sheet is new.</summary>
    SheetAdded,

    /// <summary>A limit sheet is gone.</summary>
    SheetRemoved,

    /// <summary>A setting order: targets, schools, speeds.</summary>
    Setting,

    /// <summary>A waiver.</summary>
    Waiver,

    /// <summary>Which jurisdictions the site names, and the rules that come and go with them.</summary>
    Jurisdiction,

    /// <summary>The other registers: people, locks, machines, procedures, clock.</summary>
    Register,

    /// <summary>Which text is cited for a rule. Never changes a verdict.</summary>
    Citation,

    /// <summary>Words and grounds of a rule. Never changes a verdict.</summary>
    Words,
}
