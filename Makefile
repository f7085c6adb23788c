# One virtual environment beside the project; nothing is installed elsewhere.
PYTHON ?= python3
BIN    := .venv/bin

# The theme prints an advertisement for other generators unless told not to.
export NO_MKDOCS_2_WARNING := 1
export DISABLE_MKDOCS_2_WARNING := true
# The tests begin hundreds of processes; one that must compile every module anew takes four times as long.
unexport PYTHONDONTWRITEBYTECODE

.PHONY: locked site serve lint scripts test coverage benchmarks mutants clean

site: .venv/ready
	$(BIN)/python -m generator check
	$(BIN)/mkdocs build --strict

# With FAMILY=tessaly-40 that family alone.
serve: .venv/ready
	HANDWHEEL_FAMILY="$(FAMILY)" $(BIN)/mkdocs serve

# Types, order and likely bugs, by the rules in pyproject.toml.
lint: .venv/test-ready
	$(BIN)/python -m ruff check --quiet .
	$(BIN)/python -m mypy

# The scripts against the shapes of their data; needs Node.js, and nothing else here does.
scripts:
	npx --yes --package typescript@5 tsc --project generator/jsconfig.json

# A file of tests stays in one process: what its tests share is made once. One process more than there are
# processors, for those that wait for a browser; the files in our order, so that the site is built from the start.
test: lint
	$(BIN)/python -m pytest --numprocesses $$($(BIN)/python -c "import os; print((os.cpu_count() or 1) + 1)") \
	  --dist loadfile --no-loadscope-reorder

# Which modules have a branch in twenty that no test takes; every process counts that a test begins. One test lets the
# disk run full, where there is no room for the counts either.
coverage: export COVERAGE_FILE := $(CURDIR)/build/coverage/counted
coverage: .venv/test-ready
	rm -rf build/coverage
	mkdir -p build/coverage
	nice $(BIN)/python -m coverage run -m pytest --numprocesses auto --dist loadfile --no-loadscope-reorder \
	  --deselect tests/site/test_build.py::test_a_disk_that_takes_no_more_leaves_the_last_site_alone
	$(BIN)/python -m coverage combine --quiet
	$(BIN)/python -m coverage json --quiet -o build/coverage/told.json
	$(BIN)/python -m tests.tools.untaken build/coverage/told.json

# A table of all figures at the end; with LARGE=1 also a book of 1,000 families, which takes hours.
benchmarks: .venv/test-ready
	LARGE="$(LARGE)" $(BIN)/python -m pytest tests/benchmarks --override-ini addopts=-q --override-ini timeout=0 --capture=no

# Which small faults put into these modules no test finds, for example MODULES=generator/analysis/reckon.py
MODULES ?= $(wildcard generator/analysis/*.py)
mutants: .venv/test-ready
	nice $(BIN)/python -m tests.mutants $(MODULES)

# The environment with every package at the version, and of the fingerprint, that requirements.lock names.
locked:
	$(PYTHON) -m venv --clear .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements.lock
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
	touch .venv/ready .venv/test-ready

clean:
	rm -rf .venv .cache site

.venv/ready: pyproject.toml
	$(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -e .
	touch $@

# In one go, since to find out twice what fits together takes longer; modules are compiled as they are used.
.venv/test-ready: pyproject.toml
	$(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-compile -e ".[test]"
	touch .venv/ready $@
