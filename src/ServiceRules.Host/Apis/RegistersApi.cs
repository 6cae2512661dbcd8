using System.ComponentModel;
using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Library;
using ServiceRules.Formats.Registers;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;
using ServiceRules.Rules.Checking;

namespace ServiceRules.Host.Apis;

/// <summary>What the site keeps besides its records: people, machines, instruments, procedures.</summary>
internal static class RegistersApi
{
    public static void MapRegisters(this IEndpointRouteBuilder routes)
    {
        var registers = routes.MapGroup("/api").WithTags("registers");
        Map<PersonPart>(
            registers,
            "people",
            "People of the site, as records and amendments name them.",
            (site, _) => new([.. site.People], [], [], [])
        );
        Map<MachinePart>(
            registers,
            "machines",
            "Machines, with every source of energy they have.",
            (site, _) => new([], [], [], []) { Machines = site.Machines }
        );
        Map<InstrumentPart>(
            registers,
            "instruments",
            "Gauges that the site owns.",
            (_, library) => new([], [], [], [.. library.Instruments.Select(placed => placed.Value)])
        );
        registers
            .MapGet(
                "/procedures",
                (HttpContext context, ServedSites sites, [Description(SiteText.Text)] string? site) =>
                    sites.Choose(Caller.Known(context.User), site, out var own)
                    ?? Conditional.Json(Procedures(own.Registers), context)
            )
            .WithName("listProcedures")
            .WithSummary("Written make-safe procedures.")
            .Produces<PartList<ProcedureDocument>>()
            .Complains(ProblemKind.BadRequest);
    }

    private static void Map<TPart>(
        RouteGroupBuilder registers,
        string name,
        string summary,
        Func<SiteRegisters, RuleLibrary, RegistersFile> part
    ) =>
        registers
            .MapGet(
                "/" + name,
                (HttpContext context, ServedSites sites, [Description(SiteText.Text)] string? site) =>
                    sites.Choose(Caller.Known(context.User), site, out var own)
                    ?? Conditional.Json(Part(part(own.Registers, own.Library), name), context)
            )
            .WithName("list" + char.ToUpperInvariant(name[0]) + name[1..])
            .WithSummary(summary)
            .Produces<PartList<TPart>>()
            .Complains(ProblemKind.BadRequest);

    // As `registers.json` spells them: one spelling for whoever reads both.
    private static ListAnswer Part(RegistersFile file, string name)
    {
        using var document = JsonDocument.Parse(SiteFormat.Registers.Write(file));
        return new(
            document.RootElement.TryGetProperty(name, out var items)
                ? [.. items.EnumerateArray().Select(item => item.Clone())]
                : []
        );
    }

    private static ListAnswer Procedures(SiteRegisters site) =>
        new([
            .. site.Procedures.Select(procedure =>
                JsonSerializer.Deserialize<JsonElement>(SiteFormat.Procedure.Write(procedure))
            ),
        ]);
}
