namespace ServiceRules.Rules.Model;

/// <summary>On what a rule is judged.</summary>
public enum RuleScope
{
    /// <summary>Each unit.</summary>
    Unit,

    /// <summary>The units of the machine together.</summary>
    Set,

    /// <summary>The job.</summary>
    Job,

    /// <summary>How the site runs its programme: judged with the job, told apart, and of no weight in what may go out.</summary>
    Programme,
}
