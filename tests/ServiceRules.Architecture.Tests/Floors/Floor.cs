namespace ServiceRules.Architecture.Tests.Floors;

/// <summary>One project of the product and everything it may see.</summary>
/// <param name="Name">Name of the project without its prefix.</param>
/// <param name="Below">Floors it may use.</param>
/// <param name="Libraries">Outside assemblies it may use, beyond the base class library.</param>
public sealed record Floor(string Name, string[] Below, string[] Libraries)
{
    public string ProjectName => "ServiceRules." + Name;

    /// <summary>The command line is called by its own name.</summary>
    public string AssemblyName => Name == "Cli" ? "servicerules" : ProjectName;
}
