namespace ServiceRules.Rules.Model;

/// <summary>For each of what a step is required.</summary>
public enum RequiredPer
{
    /// <summary>Once in the job.</summary>
    Job,

    /// <summary>By each person with hands in.</summary>
    Person,

    /// <summary>For each energy source.</summary>
    Source,

    /// <summary>By each person for each energy source with an isolator (a lock on a group box will do).</summary>
    PersonAndSource,
}
