namespace ServiceRules.Application.Library;

/// <summary>What a file of a folder of rules is, by its name and place.</summary>
internal enum RuleFileKind
{
    /// <summary>Nothing that is read: a mistake, unless it is put elsewhere.</summary>
    Unknown,

    /// <summary>For editors: a published schema.</summary>
    Schema,
    PackHead,
    Rules,
    Cases,
    Citations,
    FixtureRecord,
    FixtureContext,
    Sheet,
    Site,
    Registers,
    Procedure,
    SettingOrder,
}
