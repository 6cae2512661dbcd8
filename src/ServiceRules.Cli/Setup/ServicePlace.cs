namespace ServiceRules.Cli.Setup;

/// <summary>The private folder of the service where none is named.</summary>
internal static class ServicePlace
{
    // The invented shop never gets among the jobs of a real one.
    public static string Usual(bool isDemo) =>
        Path.Combine(
            Environment.GetFolderPath(
                Environment.SpecialFolder.LocalApplicationData,
                Environment.SpecialFolderOption.DoNotVerify
            ),
            "servicerules",
            isDemo ? "demo" : "service"
        );
}
