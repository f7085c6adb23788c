"""The MkDocs plugin: hooks only. What they do is in `site_build` and below."""

from __future__ import annotations

import logging
from pathlib import Path

from jinja2 import Environment
from mkdocs.config import base, config_options
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from generator import frame, frame_of_page, mkdocs_site, offline, site_build
from generator.diagrams.layout import GraphvizError
from generator.made_from import to_build, write_made_from
from generator.preview import Built, Preview
from generator.swapped_in import NewFolder

_log = logging.getLogger("mkdocs.plugins.handwheel")


class HandwheelConfig(base.Config):
    """The plugin's options in mkdocs.yml."""

    more_content = config_options.ListOfItems(config_options.Dir(exists=True), default=[])
    "Content folders laid over the first one, such as a shop's private records."
    cache = config_options.Type(str, default=".cache/handwheel")
    "Where worked-out check orders are kept between builds."
    only = config_options.Type(str, default="")
    "Families of which a preview shows the pages, so that it follows an edit in seconds; all, where none is named."


class HandwheelPlugin(BasePlugin[HandwheelConfig]):
    """Turns records into pages."""

    new: NewFolder | None = None
    "Where a build stands until it is whole."
    is_whole = False
    "Whether the last build came to its end."

    def on_startup(self, *, command: str, dirty: bool) -> None:
        """A live preview must not be kept by a browser, so it gets no service worker."""
        self.is_preview = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Point the theme at our templates, styles and scripts."""
        self.forge = mkdocs_site.forge(config)
        mkdocs_site.dress(config)
        return config

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Do all that can fail before MkDocs clears the folder of the last good site."""
        self.is_whole = False
        self.more = to_build([Path(folder) for folder in self.config.more_content])
        folders = [Path(config.docs_dir), *self.more]
        cache = Path(config.config_file_path).parent / self.config.cache
        try:
            self.only = self.config.only.split() if self.is_preview else []
            of = f" preview {' '.join(self.only)}" if self.is_preview else ""
            standing = mkdocs_site.standing(config, folders, cache, self.forge, of)
            self.site = site_build.build(folders, cache, config.site_url or "", _log.info, self.only, standing)
        except (site_build.ContentError, GraphvizError) as error:
            raise PluginError(str(error)) from None
        self.new = mkdocs_site.begin_beside(config)

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the pages, the browser's data and the assets."""
        return mkdocs_site.add_files(files, self.site, config, self.more)

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        """Keep what a page is put into its frame with."""
        self.nav = nav
        return nav

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        """Spare the theme what is the same on many pages, and what changes with the day; give pages their policy."""
        if not self.is_preview:
            frame.guard(env)
        frame.without_dates(files)
        frame.list_pages(env, files)
        frame_of_page.lay_frames(env, config)
        self.env, self.files, self.built_by = env, files, config
        return env

    def on_page_context(self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: object) -> TemplateContext:
        """Give the frame the links by which a reader says what is wrong."""
        return mkdocs_site.with_mending(context, page, self.forge)

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Give a page the scripts that it alone needs, and mark its hub."""
        return mkdocs_site.finished(output, page)

    def on_post_template(self, output: str, *, template_name: str, config: MkDocsConfig) -> str:
        """Join the script that lays the frame."""
        return frame_of_page.joined(output) if template_name == frame_of_page.SCRIPT else output

    @event_priority(-200)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Let browsers keep the whole site for use without signal, after all else is written; then publish it."""
        if not self.is_preview:
            offline.write_service_worker(Path(config.site_dir), mkdocs_site.known_prints(self.site))
            write_made_from(Path(config.site_dir), [Path(config.docs_dir), *self.more], Path(config.config_file_path).parent)
        if self.new:
            mkdocs_site.publish(self.new, config, self.site)
        self.is_whole = True

    def on_build_error(self, *, error: Exception) -> None:
        """What stood before stands; a full disk is said in one line."""
        if self.new:
            self.new.drop()
        if isinstance(error, OSError):
            raise PluginError(f"The site cannot be written: {error}. What was built before stands as it was.") from None

    def on_serve(self, server: LiveReloadServer, *, config: MkDocsConfig, **_: object) -> LiveReloadServer:
        """Follow every edit of a record, the schema or a template."""
        for folder in (*self.config.more_content, *site_build.WATCHED):
            server.watch(str(folder))
        return Preview(server.builder, self._built, [Path(config.docs_dir), *self.more], self.only).follow(server)

    def _built(self) -> Built | None:
        """The site that is shown, where the last build came to its end."""
        if not self.is_whole:
            return None
        cache = Path(self.built_by.config_file_path).parent / self.config.cache
        return Built(self.site.records, cache, self.built_by, self.files, self.nav, self.env)
