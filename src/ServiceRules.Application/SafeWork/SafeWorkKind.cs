namespace ServiceRules.Application.SafeWork;

/// <summary>What a finding about safe work is about.</summary>
public enum SafeWorkKind
{
    /// <summary>A duty of this job.</summary>
    Duty,

    /// <summary>How far the record's own entries and times can be taken at their word.</summary>
    Credibility,

    /// <summary>A register of the site: trainings, inspections, locks. Told apart from what was done on the job.</summary>
    Programme,
}
