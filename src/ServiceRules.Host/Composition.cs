using Microsoft.AspNetCore.Builder;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Demo;
using ServiceRules.Host.Description;
using ServiceRules.Host.Exports;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Limits;
using ServiceRules.Host.Pages;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Setup;
using ServiceRules.Host.Watching;

namespace ServiceRules.Host;

/// <summary>The service as a whole: what it is made of, what a request goes through, what there is to ask.</summary>
internal static class Composition
{
    public static WebApplication Of(ServiceSettings settings, ServiceFolder folder)
    {
        var builder = WebApplication.CreateSlimBuilder(
            // Another environment would show the insides of failures.
            new WebApplicationOptions
            {
                ContentRootPath = AppContext.BaseDirectory,
                EnvironmentName = "Production",
            }
        );
        builder.Listen(settings);
        builder
            .Services.AddFiling(settings, folder)
            .AddProblems()
            .AddLimits(settings.Limits)
            .AddDescription()
            .AddWatching(builder.Configuration)
            .AddPages(folder);
        if (settings.IsDemo)
        {
            builder.Services.AddDemo();
        }

        var app = builder.Build();
        app.UseHeadAsGet();
        app.UseManners();
        app.UseProblems();
        app.UseOwnNames(settings);
        app.UseSameOrigin();
        app.UseLimits();

        app.MapRecords();
        app.MapRows();
        app.MapJudgements();
        app.MapReports();
        app.MapRegisters();
        app.MapLedger();
        app.MapExports();
        app.MapDescription();
        app.MapWatching();
        app.MapPages();
        app.MapRecordPages();
        app.MapBenchPages();
        return app;
    }
}
