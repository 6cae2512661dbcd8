using System.Reflection;
using Microsoft.AspNetCore.Builder;
using ServiceRules.TestKit;

namespace ServiceRules.Architecture.Tests.Floors;

/// <summary>The floors of docs/architecture.md, those still to be built included.</summary>
internal static class House
{
    private static readonly string[] Core = ["Domain", "Rules", "Formats", "Engine", "Evidence"];

    /// <summary>Of the web and its container: the shared framework, which only the service sees.</summary>
    private static readonly string[] WebFramework =
    [
        .. Directory
            .EnumerateFiles(Path.GetDirectoryName(typeof(WebApplication).Assembly.Location)!, "*.dll")
            .Select(file => Path.GetFileNameWithoutExtension(file)!),
    ];

    public static IReadOnlyList<Floor> Floors { get; } =
    [
        new("Domain", [], ["MathNet.Numerics"]),
        new("Evidence", [], ["BouncyCastle.Cryptography"]),
        new("Rules", ["Domain"], []),
        new("Formats", ["Domain", "Rules"], []),
        new("Engine", ["Domain", "Rules"], ["NRules", "NRules.RuleModel"]),
        new("Application", Core, ["Microsoft.AspNetCore.JsonPatch.SystemTextJson"]),
        new(
            "Storage",
            [.. Core, "Application"],
            ["Microsoft.Data.Sqlite", "Npgsql", "dbup-core", "dbup-sqlite", "dbup-postgresql", "Quartz"]
        ),
        new(
            "Reporting",
            [.. Core, "Application"],
            [
                "PdfSharp",
                "PdfSharp.System",
                "PdfSharp.Shared",
                "PdfSharp.Cryptography",
                "System.Security.Cryptography.Pkcs",
            ]
        ),
        new(
            "Host",
            [.. Core, "Application", "Storage", "Reporting"],
            [
                .. WebFramework,
                "CsvHelper",
                "DocumentFormat.OpenXml",
                "DocumentFormat.OpenXml.Framework",
                "MailKit",
                "MimeKit",
                "Microsoft.AspNetCore.Authentication.OpenIdConnect",
                "Microsoft.IdentityModel.JsonWebTokens",
                "Microsoft.IdentityModel.Protocols",
                "Microsoft.IdentityModel.Protocols.OpenIdConnect",
                "Microsoft.IdentityModel.Tokens",
                "Microsoft.AspNetCore.OpenApi",
                "Microsoft.OpenApi",
                "Microsoft.Extensions.Hosting.Systemd",
                "Microsoft.Extensions.Hosting.WindowsServices",
                "OpenTelemetry",
                "OpenTelemetry.Api",
                "OpenTelemetry.Api.ProviderBuilderExtensions",
                "OpenTelemetry.Exporter.OpenTelemetryProtocol",
                "OpenTelemetry.Extensions.Hosting",
                "OpenTelemetry.Instrumentation.AspNetCore",
            ]
        ),
        new(
            "Cli",
            [.. Core, "Application", "Storage", "Reporting", "Host"],
            ["System.CommandLine", "Spectre.Console", "Spectre.Console.Ansi"]
        ),
    ];

    /// <summary>The floors that have a project today.</summary>
    public static IReadOnlyList<Floor> Built { get; } =
    [.. Floors.Where(floor => File.Exists(ProjectFile("src", floor.ProjectName)))];

    public static Floor Named(string name) => Floors.Single(floor => floor.Name == name);

    public static Assembly Compiled(Floor floor) => Assembly.Load(floor.AssemblyName);

    public static string ProjectFile(string side, string project) =>
        Path.Combine(ReferenceFiles.Root, side, project, project + ".csproj");

    public static IEnumerable<string> Projects(string side) =>
        Directory
            .EnumerateDirectories(ReferenceFiles.InRepository(side), "ServiceRules.*")
            .Select(folder => Path.GetFileName(folder)!)
            .Where(name => File.Exists(ProjectFile(side, name)));
}
