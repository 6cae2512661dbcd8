using Microsoft.AspNetCore.Builder;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Demo;
using ServiceRules.Host.Description;
using ServiceRules.Host.Due;
using ServiceRules.Host.Exports;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Inbox;
using ServiceRules.Host.Keeping;
using ServiceRules.Host.Limits;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Packs;
using ServiceRules.Host.Pages;
using ServiceRules.Host.Pages.Filed;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Providers;
using ServiceRules.Host.Rejudging;
using ServiceRules.Host.Sessions;
using ServiceRules.Host.Setup;
using ServiceRules.Host.Waiving;
using ServiceRules.Host.Watching;
using ServiceRules.Host.Working;
using ServiceRules.Storage.Inbox;

namespace ServiceRules.Host;

/// <summary>The service as a whole: what it is made of, what a request goes through, what there is to ask.</summary>
internal static class Composition
{
    public static WebApplication Of(
        ServiceSettings settings,
        ServiceFolder folder,
        InboxFolder? inbox,
        ServiceCertificate? certificate,
        NoticeSettings? notices,
        ProviderSettings? provider
    )
    {
        var builder = WebApplication.CreateSlimBuilder(
            // Another environment would show the insides of failures.
            new WebApplicationOptions
            {
                ContentRootPath = AppContext.BaseDirectory,
                EnvironmentName = "Production",
            }
        );
        builder.Listen(settings, certificate);
        builder
            .Services.AddFiling(settings, folder, notices)
            .AddProblems()
            .AddLimits(settings.Limits)
            .AddDescription()
            .AddWatching(builder.Configuration)
            .AddPages()
            .AddSessions(folder)
            .AddAccounts(folder)
            .AddProvider(provider)
            .AddKeptNotices(folder)
            .AddWork(settings, folder)
            .AddRejudging(folder)
            .AddKeeping()
            .AddDue(folder);
        if (settings.IsDemo)
        {
            builder.Services.AddDemo();
        }

        if (inbox is not null)
        {
            builder.Services.AddInbox(settings.Inbox!, inbox);
        }

        if (notices is not null)
        {
            builder.Services.AddNotices(notices);
        }

        var app = builder.Build();
        app.UseProxy(settings.Proxy);
        app.UseHeadAsGet();
        app.UseManners();
        app.UseProblems();
        app.UseOwnNames(settings, certificate);
        app.UsePublicName(settings.Proxy);
        app.UseSameOrigin();
        app.UseLimits();
        app.UseAccounts();
        app.UseAskedExactly();

        app.MapRecords();
        app.MapRows();
        app.MapJudgements();
        app.MapReports();
        app.MapVerifications();
        app.MapRegisters();
        app.MapSites();
        app.MapLedger();
        app.MapPacks();
        app.MapActivations();
        app.MapRejudging();
        app.MapExports();
        app.MapExportJobs();
        app.MapNotices();
        app.MapWaivers();
        app.MapKeeping();
        app.MapDue();
        app.MapDescription();
        app.MapWatching();
        app.MapPages();
        app.MapRecordPages();
        app.MapRecordActs();
        app.MapHoldPages();
        app.MapDuePages();
        app.MapFilePages();
        app.MapRulePages();
        app.MapWaiverPages();
        app.MapNoticePages();
        app.MapBenchPages();
        app.MapVerifyPages();
        app.MapSignInPages();
        app.MapProviderPages();
        app.MapAccountPages();
        app.MapPeoplePages();
        app.MapKeyPages();
        return app;
    }
}
