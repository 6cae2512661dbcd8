namespace ServiceRules.Domain.Tests;

/// <summary>How many random cases a property is tried with.</summary>
internal static class PropertyCases
{
#if FEW_PROPERTY_CASES
    /// <summary>Few, for mutation runs, where every test runs again for every mutant.</summary>
    public const int Each = 40;
#else
    /// <summary>The usual number.</summary>
    public const int Each = 1_000;
#endif
}
