using ServiceRules.Formats.Registers;

namespace ServiceRules.Application.Authoring;

/// <summary>What stands beside the registers of a new site: what belongs where, and what is still missing.</summary>
internal static class SiteReadme
{
    public static string Of(SiteFile site) =>
        $"""
            # {site.Name}

            What belongs to this site. The rules of the trade and the limit sheets stand in the folders beside this one.

            | file | holds | is written by |
            |---|---|---|
            | `site.json` | name, clock, jurisdictions, how locks look | made with this folder |
            | `registers.json` | people, locks, instruments, machines, waivers | `servicerules rules new person`, `lock`, `instrument`, `machine`; `servicerules rules waive` |
            | `procedures/*.json` | the written make-safe procedure of each machine and bench | the shop, from the machine's own manual; `servicerules rules new procedure` puts it into the form |
            | `setting-orders/*.json` | heights, schools and speeds from a day on | `servicerules rules order` |
            | `../sheets/*.sheet.json` | limits of each kind of unit | `servicerules rules new sheet`; those that are there are examples |

            Still missing, and nothing makes it up:

            - when each person was trained, and until when it holds: a job by somebody whose training is not stated may not go out;
            - the machines, with every source of energy each has. Somebody who knows the machine walks round it first;
            - a written procedure for each machine. A job on a machine without one is told so, and the bench page begins none;
            - the locks and tags, each with whom it is issued to;
            - the gauges;
            - a setting order with the heights of each area, and how each kind of unit is set;
            - the limit sheets of the shop's own units: the figures in `../sheets` are examples until they were held against the
              unit's own manual.

            The clock in `site.json` was computed from the zone data `{site.Zone.DataVersion}` and is kept there, so that a record reads the same
            wherever it is judged. Its last change is at {(
                site.Zone.Transitions.IsEmpty ? "no time: clocks are not moved" : site.Zone.Transitions[^1].At.ToString()
            )}; before that, and when the law on clocks changes, `servicerules rules clock` computes it anew.

            The machine's own manual, the unit's own manual, local codes and licensed practice come before anything that stands here.

            """;
}
