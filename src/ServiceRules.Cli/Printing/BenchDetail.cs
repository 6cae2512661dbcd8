namespace ServiceRules.Cli.Printing;

/// <summary>What the bench is told beyond what it needs to go on.</summary>
[Flags]
internal enum BenchDetail
{
    /// <summary>What is out or not proven, and what to do about it.</summary>
    None = 0,

    /// <summary>Also what is in, and every place that was compared.</summary>
    All = 1,

    /// <summary>Of everything measured what its uncertainty is made of.</summary>
    Budgets = 2,
}
